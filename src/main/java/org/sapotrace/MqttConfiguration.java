package org.sapotrace;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Produces;
import jakarta.inject.Singleton;
import java.util.Optional;
import org.eclipse.microprofile.config.Config;
import org.sapotrace.mqtt.MqttSettings;
import org.sapotrace.refusal.Refusal;

/** What is set about MQTT. */
@ApplicationScoped
class MqttConfiguration {

  private final Config settings;

  MqttConfiguration(Config settings) {
    this.settings = settings;
  }

  @Produces
  @Singleton
  MqttSettings mqttSettings() {
    return mqttSettings(settings);
  }

  /**
   * What {@code SAPOTRACE_MQTT_URL} and its like say.
   *
   * @throws Refusal for what cannot be
   */
  static MqttSettings mqttSettings(Config settings) {
    return MqttSettings.of(
        text(settings, "url"),
        text(settings, "username"),
        text(settings, "password"),
        text(settings, "topic"));
  }

  private static Optional<String> text(Config settings, String name) {
    return settings.getOptionalValue("sapotrace.mqtt-" + name, String.class);
  }
}
