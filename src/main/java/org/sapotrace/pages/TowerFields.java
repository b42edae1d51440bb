package org.sapotrace.pages;

import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Throughput;
import org.sapotrace.bench.Titration;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.pages.Field.Kind;

/** The fields of what went through a tower or a flush, on which forecasts rest. */
final class TowerFields {

  private static final String LITRES = "throughput.litres";
  private static final String BED_VOLUMES = "throughput.bedVolumes";
  private static final String INLET = "inletMgPerKg";

  /** What was read of them. */
  record Read(@Nullable Throughput throughput, @Nullable Double inletMgPerKg) {}

  private TowerFields() {}

  /** Those that are asked for at a sampling point, and whichever else holds something. */
  static List<Field> at(SamplingPoint point, Typed typed) {
    boolean isFlush = point == SamplingPoint.FLUSH_METHANOL;
    boolean isTower = point == SamplingPoint.AFTER_DRY_WASH;
    boolean isCounted = isFlush || isTower;
    String since = isFlush ? "Since the flush began." : "Since the bed was new.";
    return Stream.of(
            asked(isCounted, field(BED_VOLUMES, "Bed volumes gone through", since), typed),
            asked(isCounted, field(LITRES, "Litres gone through", since), typed),
            asked(
                isTower,
                field(INLET, "Soap before", "Or record it in the stream before.").in("mg/kg"),
                typed))
        .flatMap(Optional::stream)
        .toList();
  }

  private static Field field(String name, String label, String hint) {
    return Field.of(name, label, Kind.NUMBER).hinting(hint);
  }

  private static Optional<Field> asked(boolean isAsked, Field field, Typed typed) {
    return isAsked || typed.has(field.name()) ? Optional.of(field.filled(typed)) : Optional.empty();
  }

  /** Fills in what is on record of a titration. */
  static void fill(Typed typed, Titration titration) {
    Throughput throughput = titration.throughput();
    if (throughput != null) {
      typed.put(LITRES, throughput.litres());
      typed.put(BED_VOLUMES, throughput.bedVolumes());
    }
    typed.put(INLET, titration.inletMgPerKg());
  }

  static Read read(Typed typed) {
    Double litres = checked(typed, LITRES, Throughput::checkedLitres);
    Double bedVolumes = checked(typed, BED_VOLUMES, Throughput::checkedBedVolumes);
    return new Read(
        litres == null && bedVolumes == null ? null : new Throughput(litres, bedVolumes),
        checked(typed, INLET, Titration::checkedInlet));
  }

  /** The number in a field; null where it cannot be, which is then the fault of the field. */
  private static @Nullable Double checked(
      Typed typed, String field, UnaryOperator<@Nullable Double> check) {
    try {
      return check.apply(typed.number(field));
    } catch (IllegalArgumentException impossible) {
      typed.fault(field, String.valueOf(impossible.getMessage()));
      return null;
    }
  }
}
