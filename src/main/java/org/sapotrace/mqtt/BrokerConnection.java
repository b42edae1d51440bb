package org.sapotrace.mqtt;

import io.netty.handler.codec.mqtt.MqttQoS;
import io.vertx.core.Future;
import io.vertx.core.Vertx;
import io.vertx.core.buffer.Buffer;
import io.vertx.mqtt.MqttClient;
import io.vertx.mqtt.MqttClientOptions;
import io.vertx.mqtt.MqttConnectionException;
import io.vertx.mqtt.messages.MqttPublishMessage;
import java.time.Duration;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Supplier;
import javax.net.ssl.SSLException;
import org.jspecify.annotations.Nullable;

/**
 * A connection to a broker, for one thread, which waits for what it asked for before it asks for
 * more. Once it is lost, it stays so.
 */
final class BrokerConnection implements AutoCloseable {

  private static final int CONNECT_MS = 5_000;
  private static final int PATIENCE_S = 15;
  private static final int REFUSED = 0x80;

  /** The longest that MQTT knows: a longer one than the client reads would end every connection. */
  private static final int LONGEST_MESSAGE = 268_435_455;

  /**
   * So many may wait to be taken. Beyond that the connection is given up: the broker keeps the
   * rest.
   */
  private static final int MOST_WAITING = 1_000;

  private final MqttClient client;
  private final BlockingQueue<MqttPublishMessage> arrived = new LinkedBlockingQueue<>(MOST_WAITING);
  private volatile CompletableFuture<Object> reply = new CompletableFuture<>();

  private BrokerConnection(Vertx vertx, MqttClientOptions options) {
    client =
        MqttClient.create(vertx, options)
            .publishCompletionHandler(packet -> reply.complete(packet))
            .subscribeCompletionHandler(granted -> reply.complete(granted.grantedQoSLevels()))
            .closeHandler(closed -> lost())
            .exceptionHandler(unreadable -> drop())
            .publishHandler(this::arrive);
  }

  /** Connects, with a session that the broker keeps while the service is away. */
  static BrokerConnection open(Vertx vertx, MqttSettings.Broker broker, String clientId) {
    BrokerConnection connection = new BrokerConnection(vertx, options(broker, clientId));
    try {
      await(connection.client.connect(broker.port(), broker.host()).toCompletionStage());
      return connection;
    } catch (BrokerFailure failure) {
      connection.close();
      throw failure;
    }
  }

  private static MqttClientOptions options(MqttSettings.Broker broker, String clientId) {
    MqttClientOptions options =
        new MqttClientOptions()
            .setClientId(clientId)
            .setCleanSession(false)
            .setUsername(broker.username())
            .setPassword(broker.password());
    options.setAutoAck(false);
    options
        .setMaxMessageSize(LONGEST_MESSAGE)
        .setSsl(broker.secure())
        .setHostnameVerificationAlgorithm(broker.secure() ? "HTTPS" : "")
        .setConnectTimeout(CONNECT_MS);
    return options;
  }

  /**
   * Asks for messages, at least once each.
   *
   * @return whether the broker will send them
   */
  boolean subscribe(String filter) {
    Object granted = ask(() -> client.subscribe(filter, MqttQoS.AT_LEAST_ONCE.value()));
    return granted instanceof Iterable<?> levels && !levels.iterator().next().equals(REFUSED);
  }

  /** Publishes a message, and returns once the broker has it. */
  void publish(String topic, String payload) {
    Buffer body = Buffer.buffer(payload);
    ask(() -> client.publish(topic, body, MqttQoS.AT_LEAST_ONCE, false, false));
  }

  private Object ask(Supplier<Future<Integer>> request) {
    CompletableFuture<Object> answer = new CompletableFuture<>();
    reply = answer;
    await(open(request).toCompletionStage());
    return await(answer);
  }

  /** Tells the broker that it need not bring a message again. */
  void acknowledge(MqttPublishMessage message) {
    open(
        () -> {
          message.ack();
          return message;
        });
  }

  private <T> T open(Supplier<T> request) {
    requireOpen();
    try {
      return request.get();
    } catch (NullPointerException lostMeanwhile) {
      // This is what comes of the client then.
      throw new BrokerFailure("the connection was lost");
    }
  }

  /** The next message that came, if one comes in time; it is to be acknowledged. */
  @Nullable MqttPublishMessage next(Duration patience) {
    try {
      return arrived.poll(patience.toMillis(), TimeUnit.MILLISECONDS);
    } catch (InterruptedException stopping) {
      throw interrupted();
    }
  }

  private static BrokerFailure interrupted() {
    Thread.currentThread().interrupt();
    return new BrokerFailure("the service stops");
  }

  void requireOpen() {
    if (!client.isConnected()) {
      throw new BrokerFailure("the connection was lost");
    }
  }

  private void arrive(MqttPublishMessage message) {
    if (!arrived.offer(message)) {
      drop();
    }
  }

  private void lost() {
    reply.completeExceptionally(new IllegalStateException("lost"));
  }

  private void drop() {
    client.disconnect();
  }

  @Override
  public void close() {
    client.disconnect();
  }

  private static <T> T await(CompletionStage<T> stage) {
    try {
      return stage.toCompletableFuture().get(PATIENCE_S, TimeUnit.SECONDS);
    } catch (ExecutionException failed) {
      throw new BrokerFailure(reason(failed.getCause()));
    } catch (TimeoutException late) {
      throw new BrokerFailure("it did not answer in time");
    } catch (InterruptedException stopping) {
      throw interrupted();
    }
  }

  /** What the one who runs the service may do something about. */
  private static String reason(@Nullable Throwable failure) {
    if (failure instanceof MqttConnectionException refused) {
      return switch (refused.code()) {
        case CONNECTION_REFUSED_BAD_USER_NAME_OR_PASSWORD, CONNECTION_REFUSED_NOT_AUTHORIZED ->
            "it does not let this user in, so check SAPOTRACE_MQTT_USERNAME and _PASSWORD";
        default -> "it refused the connection";
      };
    }
    return failure instanceof SSLException
        ? "no secure connection came about, so check its certificate"
        : "there is no connection";
  }
}
