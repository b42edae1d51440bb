package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;

/** Tells which streams of the plant belong together. */
@ApplicationScoped
class Neighbours {

  private final ProductLines productLines;

  Neighbours(ProductLines productLines) {
    this.productLines = productLines;
  }

  /** The stream behind the wash or tower that a stream is on either side of; null for none. */
  @Nullable Stream outlet(Stream stream) {
    if (stream.isKeptRemoval()) {
      Stream outlet = named(stream, stream.outlet());
      return outlet.inlet() == null ? null : outlet;
    }
    if (stream.inlet() != null) {
      return stream;
    }
    return ofSoap(String.valueOf(stream.line())).stream()
        .filter(each -> stream.slug().equals(each.inlet()))
        .findFirst()
        .orElse(null);
  }

  /** What lies before the wash or tower of an outlet. */
  Stream inlet(Stream outlet) {
    return named(outlet, outlet.inlet());
  }

  /** What the wash or tower of an outlet removes. */
  Stream removal(Stream outlet) {
    return productLines.removals(outlet).stream()
        .filter(each -> outlet.slug().equals(each.outlet()))
        .findFirst()
        .orElseThrow();
  }

  /**
   * The only crude of a line, before washed fuel of which nobody stated what lies before it; null
   * for none or several. What comes to a tank is not the crude of the same day.
   */
  @Nullable Stream crude(Stream washed) {
    boolean isBehindWash =
        switch (washed.samplingPoint()) {
          case AFTER_WASH, AFTER_DRY_WASH -> true;
          default -> false;
        };
    if (!isBehindWash || washed.measurand() != Measurand.SOAP) {
      return null;
    }
    List<Stream> crudes =
        ofSoap(String.valueOf(washed.line())).stream()
            .filter(each -> each.samplingPoint() == SamplingPoint.CRUDE)
            .toList();
    return crudes.size() == 1 ? crudes.get(0) : null;
  }

  /** The stream behind a removal; null for a stream that is none. */
  @Nullable Stream behind(Stream removal) {
    return removal.isKeptRemoval() ? named(removal, removal.outlet()) : null;
  }

  /** The streams of a line in which soap is titrated. */
  List<Stream> ofSoap(String line) {
    return of(line).stream()
        .filter(stream -> stream.measurand() == Measurand.SOAP && !stream.isKeptRemoval())
        .toList();
  }

  /** The streams of a line that hold blanks. */
  List<Stream> ofBlanks(String line) {
    return of(line).stream()
        .filter(stream -> stream.samplingPoint() == SamplingPoint.BLANK)
        .filter(stream -> stream.unit().equals("mL"))
        .toList();
  }

  List<Line> lines() {
    return productLines.linesAfter("", Integer.MAX_VALUE);
  }

  private List<Stream> of(String line) {
    return productLines.streamsAfter(line, "", Integer.MAX_VALUE);
  }

  private Stream named(Stream neighbour, @Nullable String slug) {
    return productLines.stream(String.valueOf(neighbour.line()), String.valueOf(slug));
  }
}
