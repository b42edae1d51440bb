package org.sapotrace.forecast;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.measure.Rounding;
import org.sapotrace.productline.Stream;

/** The specification limit that soap is heading for. */
final class UpperLimit {

  private UpperLimit() {}

  /** In the unit of the stream; null where none above 0 is specified. */
  static @Nullable Double of(Stream stream, Instant at) {
    Double upper = stream.specificationAt(at).map(Specification::upper).orElse(null);
    return upper != null && upper > 0 ? upper : null;
  }

  static Outlook missing(Outlook.Kind kind, Stream stream, List<UUID> evidence) {
    return Outlook.insufficient(
            kind,
            "Nothing is specified for %s, so that there is no limit to reach."
                .formatted(stream.name()),
            evidence)
        .missing("specification.upper of the stream, above 0.");
  }

  static Outlook undetected(Outlook.Kind kind, List<UUID> evidence) {
    return Outlook.insufficient(kind, "Nobody knows what can be told from a blank here.", evidence)
        .missing("Blanks of the line, or titrations with an uncertainty.");
  }

  static String takenForDetection(double detection) {
    return "No series of blanks is known: what is above 1.645 times the standard uncertainty of the least result, %s mg/kg, was taken as told from nothing."
        .formatted(Rounding.of(detection));
  }
}
