package org.sapotrace.notice;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.webhook.Secret;

/**
 * Who is told what.
 *
 * @param url where notices go
 * @param secret what they are signed by
 * @param former what they are signed by, too, for a while; null for nothing
 * @param lines the lines whose notices are wanted, besides those of no line; null for all
 * @param types the types that are wanted; null for all
 * @param active whether anything is sent
 * @param disabled why the service itself switched it off; null where it did not
 * @param version counts the changes, from 1
 */
public record Subscription(
    String slug,
    String url,
    Secret secret,
    @Nullable Former former,
    @Nullable List<String> lines,
    @Nullable List<NoticeType> types,
    boolean active,
    @Nullable Disabled disabled,
    int version) {

  /** For so long a former secret is signed by, that a receiver may change over meanwhile. */
  static final Duration CHANGE_OVER = Duration.ofHours(24);

  /** A secret that was replaced, and until when it signs. */
  public record Former(Secret secret, Instant until) {}

  /** When and why the service switched a subscription off. */
  public record Disabled(Instant at, String reason) {}

  /** What somebody wants; {@code secret} null for the one there is, or a new one. */
  public record Wanted(
      String slug,
      String url,
      @Nullable Secret secret,
      @Nullable List<String> lines,
      @Nullable List<NoticeType> types,
      boolean active) {}

  public Subscription {
    lines = lines == null ? null : List.copyOf(lines);
    types = types == null ? null : List.copyOf(types);
  }

  /** What messages are signed by at that time. */
  List<Secret> secretsAt(Instant now) {
    return Stream.of(
            Stream.of(secret),
            former != null && now.isBefore(former.until())
                ? Stream.of(former.secret())
                : Stream.<Secret>empty())
        .flatMap(each -> each)
        .toList();
  }
}
