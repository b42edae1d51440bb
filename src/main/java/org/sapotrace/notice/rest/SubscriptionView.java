package org.sapotrace.notice.rest;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.notice.NoticeType;
import org.sapotrace.notice.Subscription;

/**
 * A subscription as it is answered.
 *
 * @param secret only where the service made it just now, and never again
 */
record SubscriptionView(
    String subscription,
    String url,
    @Nullable List<String> lines,
    @Nullable List<NoticeType> types,
    boolean active,
    Subscription.@Nullable Disabled disabled,
    @Nullable Instant formerSecretUntil,
    @Nullable String secret) {

  static SubscriptionView of(Subscription known, boolean showsSecret) {
    Subscription.Former former = known.former();
    return new SubscriptionView(
        known.slug(),
        known.url(),
        known.lines(),
        known.types(),
        known.active(),
        known.disabled(),
        former == null ? null : former.until(),
        showsSecret ? known.secret().text() : null);
  }

  static SubscriptionView of(Subscription known) {
    return of(known, false);
  }
}
