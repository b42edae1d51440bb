package org.sapotrace;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Produces;
import jakarta.inject.Singleton;
import org.eclipse.microprofile.config.Config;
import org.sapotrace.notice.NoticeSettings;
import org.sapotrace.refusal.Refusal;
import org.sapotrace.webhook.AllowedHosts;
import org.sapotrace.webhook.TargetGuard;

/** What is set about notices. */
@ApplicationScoped
class NoticeConfiguration {

  private final Config settings;

  NoticeConfiguration(Config settings) {
    this.settings = settings;
  }

  @Produces
  @Singleton
  NoticeSettings noticeSettings() {
    return noticeSettings(settings);
  }

  @Produces
  @Singleton
  TargetGuard targetGuard() {
    return new TargetGuard(allowedHosts(settings));
  }

  /**
   * Checks what is set.
   *
   * @throws Refusal for what cannot be
   */
  static void check(Config settings) {
    noticeSettings(settings);
    allowedHosts(settings);
  }

  private static NoticeSettings noticeSettings(Config settings) {
    String host = settings.getValue("quarkus.http.host", String.class);
    String here =
        "http://%s:%s"
            .formatted(
                host.contains(":") ? "[" + host + "]" : host,
                settings.getValue("quarkus.http.port", String.class));
    return NoticeSettings.of(
        settings.getOptionalValue("sapotrace.public-url", String.class).orElse(here),
        settings.getOptionalValue("sapotrace.notice-relay", String.class).orElse("on"));
  }

  private static AllowedHosts allowedHosts(Config settings) {
    String hosts =
        settings.getOptionalValue("sapotrace.notice-allowed-hosts", String.class).orElse("");
    try {
      return AllowedHosts.parse(hosts);
    } catch (IllegalArgumentException noHost) {
      throw Refusal.impossible("SAPOTRACE_NOTICE_ALLOWED_HOSTS: " + noHost.getMessage());
    }
  }
}
