package org.sapotrace.notice;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Objects;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.refusal.Refusal;
import org.sapotrace.webhook.Secret;
import org.sapotrace.webhook.TargetGuard;

/** Keeps who is told what. */
@ApplicationScoped
@Transactional
public class Subscriptions {

  /**
   * What was put.
   *
   * @param madeSecret whether the service made the secret just now
   */
  public record Put(Subscription subscription, boolean created, boolean madeSecret) {}

  private final ProductLines productLines;
  private final SubscriptionRegister register;
  private final Outbox outbox;
  private final Deliveries deliveries;
  private final TargetGuard guard;
  private final InstantSource clock;

  Subscriptions(
      ProductLines productLines,
      SubscriptionRegister register,
      Outbox outbox,
      Deliveries deliveries,
      TargetGuard guard,
      InstantSource clock) {
    this.productLines = productLines;
    this.register = register;
    this.outbox = outbox;
    this.deliveries = deliveries;
    this.guard = guard;
    this.clock = clock;
  }

  /**
   * Creates or replaces a subscription. A new secret lets the one before sign for a day as well,
   * and what waits is due at once.
   *
   * @param precondition is shown the subscription as it stands, null where there is none, and
   *     throws where the caller wants nothing changed
   * @throws Refusal where no notice may go to the address, or there is no such line
   */
  public Put put(Subscription.Wanted wanted, Consumer<@Nullable Subscription> precondition) {
    Refusal.at("#/url", () -> guard.target(wanted.url()));
    requireLines(Objects.requireNonNullElse(wanted.lines(), List.of()));
    Subscription current = register.lock(wanted.slug()).orElse(null);
    precondition.accept(current);
    Subscription next =
        current == null ? created(wanted) : changed(current, wanted, clock.instant());
    if (next.equals(current)) {
      return new Put(next, false, false);
    }
    numberWhatWasBefore();
    register.save(next);
    deliveries.wake(next.slug(), clock.instant());
    return new Put(next, current == null, current == null && wanted.secret() == null);
  }

  /**
   * What is numbered now is told as was wanted until now, and nothing of it to a new subscriber.
   */
  private void numberWhatWasBefore() {
    while (outbox.number() > 0) {
      // There may be more than are numbered at once.
    }
  }

  /** A misspelt one would never tell anything. */
  private void requireLines(List<String> lines) {
    for (int i = 0; i < lines.size(); i++) {
      try {
        productLines.line(lines.get(i));
      } catch (Refusal unknown) {
        throw Refusal.impossible("#/lines/" + i, String.valueOf(unknown.getMessage()));
      }
    }
  }

  private static Subscription created(Subscription.Wanted wanted) {
    return new Subscription(
        wanted.slug(),
        wanted.url(),
        Objects.requireNonNullElseGet(wanted.secret(), Secret::random),
        null,
        wanted.lines(),
        wanted.types(),
        wanted.active(),
        null,
        1);
  }

  private static Subscription changed(
      Subscription current, Subscription.Wanted wanted, Instant now) {
    Secret secret = Objects.requireNonNullElse(wanted.secret(), current.secret());
    Subscription.Former former =
        secret.equals(current.secret())
            ? current.former()
            : new Subscription.Former(current.secret(), now.plus(Subscription.CHANGE_OVER));
    Subscription next = replaced(current, wanted, secret, former, current.version());
    return next.equals(current)
        ? current
        : replaced(current, wanted, secret, former, current.version() + 1);
  }

  private static Subscription replaced(
      Subscription current,
      Subscription.Wanted wanted,
      Secret secret,
      Subscription.@Nullable Former former,
      int version) {
    return new Subscription(
        current.slug(),
        wanted.url(),
        secret,
        former,
        wanted.lines(),
        wanted.types(),
        wanted.active(),
        wanted.active() ? null : current.disabled(),
        version);
  }

  /** Switches a subscription off whose receiver wants nothing more. */
  void disable(String slug, String reason) {
    Subscription current = register.lock(slug).orElseThrow();
    if (current.active()) {
      register.save(
          new Subscription(
              slug,
              current.url(),
              current.secret(),
              current.former(),
              current.lines(),
              current.types(),
              false,
              new Subscription.Disabled(clock.instant(), reason),
              current.version() + 1));
    }
  }

  public Subscription subscription(String slug) {
    return register
        .subscription(slug)
        .orElseThrow(() -> Refusal.unknown("There is no subscription %s.".formatted(slug)));
  }

  public List<Subscription> after(String slugExclusive, int most) {
    return register.after(slugExclusive, most);
  }
}
