package org.sapotrace.productline;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.refusal.Refusal;

/** What becomes of a stream as somebody defines it, for the first time or anew. */
final class Redefinition {

  private Redefinition() {}

  /**
   * The stream as it is from now on.
   *
   * @param current as it was; null for a new one
   * @throws Refusal where what is on record would mean something else
   */
  static Stream of(StreamDefinition definition, Line line, @Nullable Stream current, Instant now) {
    if (current != null) {
      refuseOtherMeaning(definition, current);
    }
    String inlet =
        current != null && current.isKeptRemoval() ? current.inlet() : definition.inlet();
    List<DatedSpecification> specifications =
        new ArrayList<>(current == null ? List.of() : current.specifications());
    specification(definition, line, current, now).ifPresent(specifications::add);
    Stream next =
        new Stream(
            current == null ? RecordIdentifier.after(null, now) : current.id(),
            definition.line(),
            definition.slug(),
            definition.name(),
            definition.samplingPoint(),
            definition.measurand(),
            definition.unit(),
            inlet,
            current == null ? null : current.outlet(),
            definition.chart(),
            specifications,
            current == null ? 1 : current.version());
    return current == null || next.equals(current) ? next : next.withVersion(current.version() + 1);
  }

  /** What is on record was measured as something; it does not become something else. */
  private static void refuseOtherMeaning(StreamDefinition definition, Stream current) {
    if (definition.samplingPoint() != current.samplingPoint()
        || definition.measurand() != current.measurand()
        || !definition.unit().equals(current.unit())) {
      throw Refusal.conflict(
          "Stream %s of line %s keeps its sampling point, measurand and unit (%s, %s, %s): its results mean that. Define a new stream instead."
              .formatted(
                  current.slug(),
                  current.line(),
                  current.samplingPoint().id(),
                  current.measurand().id(),
                  current.unit()));
    }
  }

  /** The specification to be added to those on record; empty where they say it already. */
  private static Optional<DatedSpecification> specification(
      StreamDefinition definition, Line line, @Nullable Stream current, Instant now) {
    Specification limits = definition.specification();
    if (limits == null || limits.upper() == null) {
      limits = withDefaultUpper(limits, definition, line);
    }
    LocalDate today = LocalDate.ofInstant(now, ZoneOffset.UTC);
    LocalDate from = definition.specificationFrom();
    if (current == null) {
      return limits == null ? Optional.empty() : Optional.of(new DatedSpecification(limits, from));
    }
    Specification inForce =
        current.inForceOn(from == null ? today : from).map(DatedSpecification::limits).orElse(null);
    if (Objects.equals(inForce, limits)) {
      return Optional.empty();
    }
    return Optional.of(new DatedSpecification(limits, from == null ? today : from));
  }

  private static @Nullable Specification withDefaultUpper(
      @Nullable Specification given, StreamDefinition definition, Line line) {
    if (definition.measurand() != Measurand.SOAP || !definition.samplingPoint().hasSoapDefault()) {
      return given;
    }
    Double upper = Specification.soapDefault(line.alkali()).upper();
    return Refusal.at(
        "#/specification", () -> new Specification(given == null ? null : given.lower(), upper));
  }
}
