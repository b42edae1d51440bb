package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.enterprise.event.Observes;
import jakarta.transaction.Transactional;
import java.time.InstantSource;
import java.util.List;
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
  private final LimitsFactory factory;
  private final Judge judge;
  private final InstantSource clock;
  private final Event<LimitsAdopted> adoption;

  Limits(
      ProductLines productLines,
      Points points,
      LimitsRevisions limitsRevisions,
      LimitsFactory factory,
      Judge judge,
      InstantSource clock,
      Event<LimitsAdopted> adoption) {
    this.productLines = productLines;
    this.points = points;
    this.limitsRevisions = limitsRevisions;
    this.factory = factory;
    this.judge = judge;
    this.clock = clock;
    this.adoption = adoption;
  }

  /**
   * Lays down limits of somebody's choice.
   *
   * @throws Refusal if they cannot be had from what is on record
   */
  public LimitsRevision adopt(String line, String slug, NewLimits wanted) {
    Stream stream = productLines.lock(line, slug);
    LimitsRevision adopted =
        factory.adopted(stream, limitsRevisions.of(stream.id()), wanted, clock.instant());
    layDown(stream, adopted);
    adoption.fire(new LimitsAdopted(stream, adopted));
    return adopted;
  }

  /** A stream that is charted otherwise from now on gets a revision of its own. */
  void follow(@Observes ProductLines.ChartSettingsChanged change) {
    Stream stream = change.stream();
    factory
        .afterChange(stream, limitsRevisions.of(stream.id()), change.at())
        .forEach(revision -> layDown(stream, revision));
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
