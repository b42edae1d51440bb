package org.sapotrace.mqtt;

import java.net.URI;
import java.net.URISyntaxException;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.sapotrace.refusal.Refusal;

/**
 * What is set about MQTT.
 *
 * @param broker null where there is none
 * @param prefix the first levels of every topic
 */
public record MqttSettings(@Nullable Broker broker, String prefix) {

  public static final String DEFAULT_PREFIX = "sapotrace/v1";

  private static final Pattern PREFIX =
      Pattern.compile("[^+#$/\\s\\p{Cntrl}]+(/[^+#$/\\s\\p{Cntrl}]+)*");
  private static final int LONGEST_PREFIX = 200;

  /**
   * Where the broker is, and as whom the service signs in.
   *
   * @param username null for nobody
   * @param password null for none
   */
  record Broker(
      boolean secure, String host, int port, @Nullable String username, @Nullable String password) {

    /** The address alone, as it goes into logs. */
    @Override
    public String toString() {
      return "%s://%s:%d"
          .formatted(secure ? "mqtts" : "mqtt", host.contains(":") ? "[" + host + "]" : host, port);
    }
  }

  /**
   * The settings of that text.
   *
   * @throws Refusal where one says nothing that it can say
   */
  public static MqttSettings of(
      Optional<String> url,
      Optional<String> username,
      Optional<String> password,
      Optional<String> topic) {
    String prefix = topic.orElse(DEFAULT_PREFIX);
    if (url.isEmpty()) {
      return new MqttSettings(null, prefix);
    }
    if (!PREFIX.matcher(prefix).matches() || prefix.length() > LONGEST_PREFIX) {
      throw Refusal.impossible(
          "SAPOTRACE_MQTT_TOPIC is \"%s\": set the first levels of the topics, such as %s, without +, #, $, blanks or a slash at either end."
              .formatted(prefix, DEFAULT_PREFIX));
    }
    if (password.isPresent() && username.isEmpty()) {
      throw Refusal.impossible(
          "SAPOTRACE_MQTT_PASSWORD is set without a user: set SAPOTRACE_MQTT_USERNAME as well.");
    }
    return new MqttSettings(
        broker(url.get(), username.orElse(null), password.orElse(null)), prefix);
  }

  private static Broker broker(String url, @Nullable String username, @Nullable String password) {
    try {
      URI address = new URI(url);
      boolean secure = "mqtts".equals(address.getScheme());
      if (address.getHost() != null
          && (secure || "mqtt".equals(address.getScheme()))
          && address.getPort() != 0
          && address.getPort() <= 65_535
          && address.getRawUserInfo() == null
          && address.getRawPath().matches("/?")
          && address.getRawQuery() == null
          && address.getRawFragment() == null) {
        int usual = secure ? 8883 : 1883;
        int port = address.getPort() == -1 ? usual : address.getPort();
        return new Broker(
            secure, address.getHost().replaceAll("[\\[\\]]", ""), port, username, password);
      }
    } catch (URISyntaxException unreadable) {
      // Refused below, without the value: it may hold a password.
    }
    throw Refusal.impossible(
        "SAPOTRACE_MQTT_URL is no address of a broker: set one such as mqtts://broker.plant.example:8883, with user and password in SAPOTRACE_MQTT_USERNAME and SAPOTRACE_MQTT_PASSWORD.");
  }
}
