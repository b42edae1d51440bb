package org.sapotrace.notice.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.NullUnmarked;
import org.sapotrace.notice.NoticeType;
import org.sapotrace.notice.Subscription;
import org.sapotrace.webhook.Secret;

@Entity
@Table(name = "subscription")
@NullUnmarked
class SubscriptionEntity {

  @Id String slug;
  String url;
  String secret;

  @Column(name = "former_secret")
  String formerSecret;

  @Column(name = "former_secret_until")
  Instant formerSecretUntil;

  String[] lines;
  String[] types;
  boolean active;

  @Column(name = "disabled_at")
  Instant disabledAt;

  @Column(name = "disabled_reason")
  String disabledReason;

  int version;

  void take(Subscription subscription) {
    Subscription.Former former = subscription.former();
    Subscription.Disabled disabled = subscription.disabled();
    List<NoticeType> wanted = subscription.types();
    slug = subscription.slug();
    url = subscription.url();
    secret = subscription.secret().text();
    formerSecret = former == null ? null : former.secret().text();
    formerSecretUntil = former == null ? null : former.until();
    lines = subscription.lines() == null ? null : subscription.lines().toArray(String[]::new);
    types = wanted == null ? null : wanted.stream().map(NoticeType::id).toArray(String[]::new);
    active = subscription.active();
    disabledAt = disabled == null ? null : disabled.at();
    disabledReason = disabled == null ? null : disabled.reason();
    version = subscription.version();
  }

  Subscription toSubscription() {
    return new Subscription(
        slug,
        url,
        Secret.parse(secret),
        formerSecret == null
            ? null
            : new Subscription.Former(Secret.parse(formerSecret), formerSecretUntil),
        lines == null ? null : List.of(lines),
        types == null ? null : Stream.of(types).map(NoticeType::named).toList(),
        active,
        disabledAt == null ? null : new Subscription.Disabled(disabledAt, disabledReason),
        version);
  }
}
