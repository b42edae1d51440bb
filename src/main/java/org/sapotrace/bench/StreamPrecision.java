package org.sapotrace.bench;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.OwnReplicates.Determined;
import org.sapotrace.bench.OwnReplicates.Search;
import org.sapotrace.monitoring.Limits;
import org.sapotrace.monitoring.LimitsRevision;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Tells how precise the titrations of the streams are. */
@ApplicationScoped
@Transactional
public class StreamPrecision {

  private static final int MOST = 1000;

  /** How far back titrations are looked for among results that were measured elsewhere. */
  private static final int LOOKED = 20_000;

  /** A stream with what is to be said of it. */
  public record Told(Stream stream, PrecisionReport report) {}

  private final ProductLines productLines;
  private final OwnReplicates replicates;
  private final Limits limits;

  StreamPrecision(ProductLines productLines, OwnReplicates replicates, Limits limits) {
    this.productLines = productLines;
    this.replicates = replicates;
    this.limits = limits;
  }

  /**
   * The precision of a stream's titrations, of the latest thousand at most.
   *
   * @param from first time of sampling, inclusive; null for no bound
   * @param to last time of sampling, inclusive; null for no bound
   * @throws Refusal if there is no such stream
   */
  public Told of(String line, String slug, @Nullable Instant from, @Nullable Instant to) {
    Stream stream = productLines.stream(line, slug);
    List<Determined> found =
        replicates.latest(stream.id(), new Search(from, to, 1, LOOKED, MOST + 1));
    List<Determined> latest = found.subList(Math.max(0, found.size() - MOST), found.size());
    PrecisionReview review = new PrecisionReview(latest, inForce(stream, latest), stream.unit());
    if (found.size() > MOST) {
      review.caution(
          "There are more titrations: the latest %d were looked at. Ask for earlier ones by their dates."
              .formatted(MOST));
    }
    return new Told(stream, review.report());
  }

  /** The limits that judge the last of some samples. */
  private @Nullable LimitsRevision inForce(Stream stream, List<Determined> latest) {
    return latest.isEmpty()
        ? null
        : limits.inForce(stream, latest.get(latest.size() - 1).sampledAt()).orElse(null);
  }
}
