package org.sapotrace.notice.persistence;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.notice.NoticeType;
import org.sapotrace.notice.Subscription;

/** What the ledger holds of a subscription: all but what its messages are signed by. */
record SubscriptionEntry(
    String url,
    @Nullable List<String> lines,
    @Nullable List<NoticeType> types,
    boolean active,
    Subscription.@Nullable Disabled disabled,
    int version) {

  static SubscriptionEntry of(Subscription subscription) {
    return new SubscriptionEntry(
        subscription.url(),
        subscription.lines(),
        subscription.types(),
        subscription.active(),
        subscription.disabled(),
        subscription.version());
  }
}
