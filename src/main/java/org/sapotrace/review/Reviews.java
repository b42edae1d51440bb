package org.sapotrace.review;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.InstantSource;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Samples;
import org.sapotrace.chartimage.Block;
import org.sapotrace.chartimage.Paper;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.refusal.Refusal;

/** Writes reviews of lines. */
@ApplicationScoped
@Transactional
public class Reviews {

  private final ProductLines productLines;
  private final Samples samples;
  private final Gathering gathering;
  private final InstantSource clock;

  Reviews(ProductLines productLines, Samples samples, Gathering gathering, InstantSource clock) {
    this.productLines = productLines;
    this.samples = samples;
    this.gathering = gathering;
    this.clock = clock;
  }

  /**
   * The period that is asked for, where it is not said in full: up to the latest result, and the
   * usual time before that.
   *
   * @param from its first time of sampling, inclusive; null for the usual time before its end
   * @param to its last time of sampling, inclusive; null for that of the latest result
   * @throws IllegalArgumentException where that is no period, or too long a one
   * @throws Refusal if there is no such line
   */
  public Period period(String line, @Nullable Instant from, @Nullable Instant to) {
    productLines.line(line);
    Instant end = to == null ? latest(line) : to;
    return new Period(from == null ? end.minus(Period.USUAL) : from, end);
  }

  /** When the latest sample was taken; of a line without results, when the day began. */
  private Instant latest(String line) {
    return productLines.streamsAfter(line, "", Integer.MAX_VALUE).stream()
        .flatMap(each -> samples.latest(each.id(), new Samples.Search(null, false, 1)).stream())
        .map(Samples.Sample::sampledAt)
        .max(Comparator.naturalOrder())
        .orElseGet(() -> clock.instant().truncatedTo(ChronoUnit.DAYS));
  }

  /**
   * The review of a line in a period.
   *
   * @throws Refusal if there is no such line, or too much for a review
   */
  public Paper of(String slug, Period period) {
    Line line = productLines.line(slug);
    LineReview review = gathering.of(line, period);
    List<Block> blocks = new ArrayList<>(new Summary(review).blocks());
    review.streams().forEach(stream -> blocks.addAll(new StreamChapter(stream).blocks()));
    blocks.addAll(new TitrantChapter(review).blocks());
    blocks.addAll(new LastPart(review).blocks());
    String days = "%s to %s".formatted(Words.day(period.from()), Words.day(period.to()));
    return new Paper(
        "Review of %s, %s".formatted(line.name(), days),
        "%s, %s (UTC)".formatted(line.name(), days),
        Objects.requireNonNullElse(review.lastSampledAt(), period.to()),
        blocks);
  }
}
