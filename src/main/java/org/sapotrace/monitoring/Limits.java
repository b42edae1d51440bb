package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.enterprise.event.Observes;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.InstantSource;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Lays down the limits of the streams, and tells them. */
@ApplicationScoped
@Transactional
public class Limits {

  private final ProductLines productLines;
  private final Points points;
  private final LimitsRevisions limitsRevisions;
  private final Regimes regimes;
  private final LimitsFactory factory;
  private final Judge judge;
  private final InstantSource clock;
  private final Event<LimitsAdopted> adoption;

  Limits(
      ProductLines productLines,
      Points points,
      LimitsRevisions limitsRevisions,
      Regimes regimes,
      LimitsFactory factory,
      Judge judge,
      InstantSource clock,
      Event<LimitsAdopted> adoption) {
    this.productLines = productLines;
    this.points = points;
    this.limitsRevisions = limitsRevisions;
    this.regimes = regimes;
    this.factory = factory;
    this.judge = judge;
    this.clock = clock;
    this.adoption = adoption;
  }

  /**
   * Lays down limits of somebody's choice; from the same baseline those of the stream's removal,
   * where that is watched and its results suffice.
   *
   * @throws Refusal if they cannot be had from what is on record
   */
  public LimitsRevision adopt(String line, String slug, NewLimits wanted) {
    Stream stream = productLines.lock(line, slug);
    LimitsRevision adopted = factory.adopted(stream, regimes.of(stream), wanted, clock.instant());
    for (Stream removal : productLines.lockRemovals(stream)) {
      if (stream.slug().equals(removal.outlet()) && adopted.baseline() != null) {
        adopted = withThoseOf(removal, stream, wanted, adopted, adopted.baseline());
      }
    }
    layDownAdopted(stream, adopted);
    return adopted;
  }

  /**
   * Lays down the same of a removal stream; answers what was adopted, telling where that failed.
   */
  private LimitsRevision withThoseOf(
      Stream removal,
      Stream outlet,
      NewLimits wanted,
      LimitsRevision adopted,
      LimitsRevision.Baseline baseline) {
    NewLimits same =
        new NewLimits(
            new NewLimits.Period(baseline.from(), baseline.to()),
            null,
            sameSamples(removal, outlet, adopted.excluded(), baseline),
            wanted.effectiveFrom(),
            wanted.reason(),
            wanted.reestimateAt());
    try {
      layDownAdopted(
          removal, factory.adopted(removal, regimes.of(removal), same, adopted.adoptedAt()));
      return adopted;
    } catch (Refusal none) {
      return adopted.advising(
          "Adopt limits of stream %s by themselves, which stay as they are: %s"
              .formatted(removal.slug(), none.getMessage()));
    }
  }

  /** The removals of the samples that are left out of a baseline of the outlet. */
  private List<Exclusion> sameSamples(
      Stream removal, Stream outlet, List<Exclusion> excluded, LimitsRevision.Baseline baseline) {
    List<ChartedResult> chosen =
        points.between(removal.id(), baseline.from(), baseline.to()).stream()
            .map(Point::result)
            .toList();
    Map<UUID, Exclusion> same = new LinkedHashMap<>();
    for (Exclusion each : excluded) {
      ChartedResult out = points.ofResult(outlet.id(), each.result()).orElseThrow().result();
      chosen.stream()
          .filter(r -> r.batch().equals(out.batch()) && r.sampledAt().equals(out.sampledAt()))
          .forEach(r -> same.put(r.result(), new Exclusion(r.result(), each.cause(), null)));
    }
    return List.copyOf(same.values());
  }

  /** A stream that is charted otherwise from now on gets a revision of its own. */
  void follow(@Observes ProductLines.ChartSettingsChanged change) {
    Stream stream = change.stream();
    LaidDownAgain.underNewRules(stream, regimes.of(stream), change.at())
        .forEach(revision -> layDown(stream, revision));
  }

  private void layDownAdopted(Stream stream, LimitsRevision limits) {
    layDown(stream, limits);
    adoption.fire(new LimitsAdopted(stream, limits));
  }

  private void layDown(Stream stream, LimitsRevision limits) {
    limitsRevisions.add(stream.id(), limits);
    points
        .firstSince(stream.id(), limits.effectiveFrom())
        .ifPresent(
            point ->
                judge.lookBack(
                    stream, point, "limits revision %d took over".formatted(limits.revision())));
  }

  /** The limits that judge a sample taken then; empty where none do. */
  public Optional<LimitsRevision> inForce(Stream stream, Instant sampledAt) {
    return regimes.of(stream).inForce(sampledAt);
  }

  public List<LimitsRevision> of(String line, String stream) {
    return limitsRevisions.of(productLines.stream(line, stream).id());
  }

  public LimitsRevision of(String line, String stream, int revision) {
    return of(productLines.stream(line, stream), revision);
  }

  /**
   * The limits of a stream by their revision.
   *
   * @throws Refusal if it has none of that number
   */
  LimitsRevision of(Stream stream, int revision) {
    return limitsRevisions.of(stream.id()).stream()
        .filter(limits -> limits.revision() == revision)
        .findFirst()
        .orElseThrow(
            () ->
                Refusal.unknown(
                    "Stream %s%s has no limits revision %d."
                        .formatted(
                            stream.slug(),
                            stream.line() == null ? "" : " of line " + stream.line(),
                            revision)));
  }
}
