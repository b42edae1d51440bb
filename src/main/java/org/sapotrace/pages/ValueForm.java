package org.sapotrace.pages;

import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.MeasuredElsewhere;
import org.sapotrace.controlchart.Subgroup;
import org.sapotrace.pages.Field.Kind;
import org.sapotrace.productline.Stream;

/** The form of a value that was measured elsewhere, or of the values of a subgroup. */
public final class ValueForm extends EntryForm {

  static final String VALUE = "values.1";

  private static final String EXPANDED = "expandedUncertainty";
  private static final String FACTOR = "coverageFactor";
  private static final String SOURCE = "source";
  private static final double LARGEST = 1e100;
  private static final double LARGEST_FACTOR = 100;

  private final String unit;
  private final boolean ofSubgroups;

  /**
   * A form with what was typed into it.
   *
   * @param stream that the value is of
   */
  ValueForm(Typed typed, Stream stream, SampleFields sample) {
    super(typed, sample);
    unit = Words.unit(stream.unit());
    ofSubgroups = stream.chart().isOfSubgroups();
  }

  /** Writes the values of a result into a form. */
  static void fill(Typed typed, List<Double> values) {
    typed.put(VALUE, values.stream().map(DecimalText::write).collect(Collectors.joining(" ")));
  }

  public List<Field> value() {
    Field value =
        ofSubgroups
            ? Field.of(VALUE, "Values", Kind.NEEDED_TEXT)
                .hinting("One, or several with a space between them; their mean is the result.")
            : Field.of(VALUE, "Value", Kind.NEEDED_NUMBER);
    return java.util.stream.Stream.of(
            value.in(unit),
            Field.of(EXPANDED, "± expanded uncertainty", Kind.NUMBER).in(unit),
            Field.of(FACTOR, "Coverage factor k", Kind.NUMBER).hinting("2 if left empty."),
            Field.of(SOURCE, "Where it was measured", Kind.TEXT))
        .map(field -> field.filled(typed()))
        .toList();
  }

  /** What was measured alone, for a correction: the rest stays as it was. */
  public Field valueAlone() {
    return value().get(0);
  }

  @Override
  java.util.stream.Stream<Field> fieldsOfEntry() {
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
    List<Double> values = readValues();
    Double expanded = within(EXPANDED, 0, LARGEST);
    Double factor = within(FACTOR, 1, LARGEST_FACTOR);
    String source = typed.optional(SOURCE, 200);
    if (typed.isFaulty() || values == null || sampledAt == null) {
      return null;
    }
    return new MeasuredElsewhere(batch, sampledAt, values, expanded, factor, source);
  }

  /** What was measured alone; null where something is wrong with it. */
  @Nullable List<Double> readValues() {
    if (!typed().has(VALUE)) {
      typed().fault(VALUE, "What was measured?");
      return null;
    }
    return typed().read(VALUE, this::values);
  }

  private List<Double> values(String text) {
    String[] texts = ofSubgroups ? text.split("[\\s;]+") : new String[] {text};
    return new Subgroup(
            Arrays.stream(texts)
                .map(each -> checked(DecimalText.parse(each), -LARGEST, LARGEST))
                .toList())
        .values();
  }

  private @Nullable Double within(String field, double least, double most) {
    return typed().has(field)
        ? typed().read(field, text -> checked(DecimalText.parse(text), least, most))
        : null;
  }

  private static double checked(double value, double least, double most) {
    if (value >= least && value <= most) {
      return value;
    }
    throw new IllegalArgumentException(
        "Give a number from %s to %s.".formatted(words(least), words(most)));
  }

  private static String words(double bound) {
    return Math.abs(bound) == LARGEST ? (bound < 0 ? "−" : "") + "10¹⁰⁰" : DecimalText.write(bound);
  }
}
