package org.sapotrace.productline;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
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
 * @param line the slug of its line
 * @param slug its name in addresses, unique within the line
 * @param name its name for people
 * @param unit UCUM code of the unit of its results
 * @param specifications all that ever held, in the order in which they were recorded
 * @param version counts the changes, from 1
 */
public record Stream(
    UUID id,
    String line,
    String slug,
    String name,
    SamplingPoint samplingPoint,
    Measurand measurand,
    String unit,
    ChartSettings chart,
    List<DatedSpecification> specifications,
    int version) {

  public Stream {
    specifications = List.copyOf(specifications);
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
        id, line, slug, name, samplingPoint, measurand, unit, chart, specifications, newVersion);
  }

  private static boolean startsEarlier(@Nullable LocalDate day, @Nullable LocalDate other) {
    return other != null && (day == null || day.isBefore(other));
  }
}
