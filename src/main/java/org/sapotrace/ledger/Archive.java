package org.sapotrace.ledger;

import io.quarkus.narayana.jta.runtime.TransactionConfiguration;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.InstantSource;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.refusal.Refusal;

/** Shows the ledger. */
@ApplicationScoped
@Transactional
public class Archive {

  /** How long a check of all of it may take, in s. */
  private static final int LONGEST_CHECK = 900;

  private final Entries entries;
  private final Heads heads;
  private final Checked checked;
  private final LinesShown lines;
  private final InstantSource clock;

  Archive(Entries entries, Heads heads, Checked checked, LinesShown lines, InstantSource clock) {
    this.entries = entries;
    this.heads = heads;
    this.checked = checked;
    this.lines = lines;
    this.clock = clock;
  }

  /**
   * Entries in the order of their heads, all that was committed before the call among them.
   *
   * @param exclusive behind which to begin; null for the beginning
   * @param line of a line only; null for all that are shown to the caller
   * @param stream of streams of that slug only; null for any
   * @throws Refusal where there is no such line or stream, or it is not shown to the caller
   */
  public List<Entries.Read> after(
      Entries.@Nullable Place exclusive, @Nullable String line, @Nullable String stream, int most) {
    heads.make(clock.instant());
    Set<String> shown = shown(line, stream);
    return shown != null && shown.isEmpty()
        ? List.of()
        : entries.after(
            Objects.requireNonNullElse(exclusive, Entries.Place.BEGINNING),
            new Entries.Filter(shown, stream),
            most);
  }

  /** Who adopted limits of a stream that the caller may look at, and who changed its results. */
  public List<Entries.Done> changes(UUID stream) {
    return entries.changes(stream);
  }

  /**
   * Checks the whole ledger.
   *
   * @throws Refusal where the caller is kept to some of the lines
   */
  @TransactionConfiguration(timeout = LONGEST_CHECK)
  public Verification verification() {
    lines
        .slugs()
        .ifPresent(
            slugs -> {
              throw Refusal.forbidden(
                  "The ledger is checked as a whole, and the key is for %s only: use a key for all lines."
                      .formatted(String.join(", ", new TreeSet<>(slugs))));
            });
    return checked.verification();
  }

  private @Nullable Set<String> shown(@Nullable String line, @Nullable String stream) {
    Optional<Set<String>> reach = lines.slugs();
    if (line == null) {
      return reach.orElse(null);
    }
    boolean isHidden = reach.isPresent() && !reach.get().contains(line);
    if (isHidden || !lines.isLine(line)) {
      throw Refusal.unknown("There is no line %s.".formatted(line));
    }
    if (stream != null && !lines.isStream(line, stream)) {
      throw Refusal.unknown("Line %s has no stream %s.".formatted(line, stream));
    }
    return Set.of(line);
  }
}
