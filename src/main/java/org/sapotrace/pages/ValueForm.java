package org.sapotrace.pages;

import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.MeasuredElsewhere;
import org.sapotrace.pages.Field.Kind;

/** The form of a value that was measured elsewhere. */
public final class ValueForm extends EntryForm {

  static final String VALUE = "values.1";

  private static final String EXPANDED = "expandedUncertainty";
  private static final String FACTOR = "coverageFactor";
  private static final String SOURCE = "source";
  private static final double LARGEST = 1e100;
  private static final double LARGEST_FACTOR = 100;

  private final String unit;

  /**
   * A form with what was typed into it.
   *
   * @param unit of the value, as people read it
   */
  ValueForm(Typed typed, String unit, SampleFields sample) {
    super(typed, sample);
    this.unit = unit;
  }

  public List<Field> value() {
    return Stream.of(
            Field.of(VALUE, "Value", Kind.NEEDED_NUMBER).in(unit),
            Field.of(EXPANDED, "± expanded uncertainty", Kind.NUMBER).in(unit),
            Field.of(FACTOR, "Coverage factor k", Kind.NUMBER).hinting("2 if left empty."),
            Field.of(SOURCE, "Where it was measured", Kind.TEXT))
        .map(field -> field.filled(typed()))
        .toList();
  }

  /** The value alone, for a correction: the rest stays as it was. */
  public Field valueAlone() {
    return value().get(0);
  }

  @Override
  Stream<Field> fieldsOfEntry() {
    return value().stream();
  }

  @Override
  int numberOf(int index) {
    return index + 1;
  }

  @Override
  @Nullable MeasuredElsewhere read() {
    Typed typed = typed();
    String batch = SampleFields.batch(typed);
    Instant sampledAt = sampleFields().sampledAt(typed);
    Double value = readValue();
    Double expanded = within(EXPANDED, 0, LARGEST);
    Double factor = within(FACTOR, 1, LARGEST_FACTOR);
    String source = typed.optional(SOURCE, 200);
    if (typed.isFaulty() || value == null || sampledAt == null) {
      return null;
    }
    return new MeasuredElsewhere(batch, sampledAt, List.of(value), expanded, factor, source);
  }

  /** The value alone; null where something is wrong with it. */
  @Nullable Double readValue() {
    if (!typed().has(VALUE)) {
      typed().fault(VALUE, "What was measured?");
    }
    return within(VALUE, -LARGEST, LARGEST);
  }

  private @Nullable Double within(String field, double least, double most) {
    Double value = typed().number(field);
    if (value != null && !(value >= least && value <= most)) {
      typed().fault(field, "Give a number from %s to %s.".formatted(words(least), words(most)));
    }
    return value;
  }

  private static String words(double bound) {
    return Math.abs(bound) == LARGEST ? (bound < 0 ? "−" : "") + "10¹⁰⁰" : DecimalText.write(bound);
  }
}
