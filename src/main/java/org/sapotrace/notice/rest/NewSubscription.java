package org.sapotrace.notice.rest;

import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.SafeText;
import org.sapotrace.http.Slug;
import org.sapotrace.notice.NoticeType;
import org.sapotrace.notice.Subscription;
import org.sapotrace.refusal.Refusal;
import org.sapotrace.webhook.Secret;

/** A subscription as a client puts it. */
record NewSubscription(
    @NotNull @SafeText(max = 2000) String url,
    @SafeText(max = 200) @Nullable String secret,
    @Size(min = 1, max = 1000) @Nullable List<@NotNull @Slug String> lines,
    @Size(min = 1, max = 100) @Nullable List<@NotNull NoticeType> types,
    @Nullable Boolean active) {

  Subscription.Wanted toWanted(String slug) {
    return new Subscription.Wanted(
        slug,
        url,
        secret == null ? null : Refusal.at("#/secret", () -> Secret.parse(secret)),
        lines,
        types,
        active == null || active);
  }
}
