package org.sapotrace.productline;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.chemistry.Specification;

/**
 * One measurand at one sampling point of a line: what is charted.
 *
 * @param id its identifier in the record
 * @param line the slug of its line; null for one that the service keeps under no line
 * @param slug its name in addresses, unique within the line, or among those under no line
 * @param name its name for people
 * @param unit UCUM code of the unit of its results
 * @param inlet the slug of the stream of its line that lies before the wash or tower; on a removal
 *     stream, of the one that the outlet is compared with; null for none
 * @param outlet on a removal stream, which the service keeps itself, the slug of the stream behind
 *     the wash or tower; null on all others
 * @param specifications all that ever held, in the order in which they were recorded
 * @param version counts the changes, from 1
 */
public record Stream(
    UUID id,
    @Nullable String line,
    String slug,
    String name,
    SamplingPoint samplingPoint,
    Measurand measurand,
    String unit,
    @Nullable String inlet,
    @Nullable String outlet,
    ChartSettings chart,
    List<DatedSpecification> specifications,
    int version) {

  public Stream {
    specifications = List.copyOf(specifications);
  }

  /** A stream that stands under no line. */
  static Stream underNoLine(
      UUID id, String slug, String name, Measurand measurand, Specification limits) {
    return new Stream(
        id,
        null,
        slug,
        name,
        SamplingPoint.OTHER,
        measurand,
        measurand.unit().orElseThrow(),
        null,
        null,
        ChartSettings.DEFAULT,
        List.of(new DatedSpecification(limits, null)),
        1);
  }

  /** The stream of what is removed between the inlet of a stream and itself. */
  static Stream removal(UUID id, Stream outlet, String slug, String name) {
    return new Stream(
        id,
        outlet.line,
        slug,
        name,
        outlet.samplingPoint,
        Measurand.REMOVAL,
        Measurand.REMOVAL.unit().orElseThrow(),
        outlet.inlet,
        outlet.slug,
        ChartSettings.DEFAULT,
        List.of(),
        1);
  }

  /** Whether the service keeps it itself, as the removal between an inlet and an outlet. */
  public boolean isKeptRemoval() {
    return outlet != null;
  }

  /**
   * Whether throughput is counted from 0 again: a tower's since its bed is new, whatever flushed it
   * meanwhile, and a flush's since it began.
   */
  boolean isCountedAnewBy(PlantEvent.Kind kind) {
    return kind == PlantEvent.Kind.MEDIA_CHANGE
        || (kind == PlantEvent.Kind.MAINTENANCE && samplingPoint == SamplingPoint.FLUSH_METHANOL);
  }

  /** A figure with the unit as people write it: UCUM has 1 for a plain number. */
  public String withUnit(String figure) {
    return unit.equals("1") ? figure : figure + " " + unit;
  }

  /** The removal stream with that inlet and name. */
  Stream following(@Nullable String newInlet, String newName) {
    Stream next =
        new Stream(
            id,
            line,
            slug,
            newName,
            samplingPoint,
            measurand,
            unit,
            newInlet,
            outlet,
            chart,
            specifications,
            version);
    return next.equals(this) ? this : next.withVersion(version + 1);
  }

  /** The stream with one more specification, unless that is the one recorded last. */
  Stream meeting(DatedSpecification next) {
    List<DatedSpecification> all = new ArrayList<>(specifications);
    if (!all.isEmpty() && all.get(all.size() - 1).equals(next)) {
      return this;
    }
    all.add(next);
    return new Stream(
        id,
        line,
        slug,
        name,
        samplingPoint,
        measurand,
        unit,
        inlet,
        outlet,
        chart,
        all,
        version + 1);
  }

  /** The specification for a sample taken at that time; empty where nothing was specified. */
  public Optional<Specification> specificationAt(Instant sampledAt) {
    return inForceOn(LocalDate.ofInstant(sampledAt, ZoneOffset.UTC))
        .map(DatedSpecification::limits);
  }

  /**
   * The entry in force on a day: of those that began by then the one that began last, and of those
   * that began together the one recorded last.
   */
  public Optional<DatedSpecification> inForceOn(LocalDate day) {
    return specifications.stream()
        .filter(specification -> specification.holdsOn(day))
        .reduce((chosen, next) -> startsEarlier(next.from(), chosen.from()) ? chosen : next);
  }

  Stream withVersion(int newVersion) {
    return new Stream(
        id,
        line,
        slug,
        name,
        samplingPoint,
        measurand,
        unit,
        inlet,
        outlet,
        chart,
        specifications,
        newVersion);
  }

  private static boolean startsEarlier(@Nullable LocalDate day, @Nullable LocalDate other) {
    return other != null && (day == null || day.isBefore(other));
  }
}
