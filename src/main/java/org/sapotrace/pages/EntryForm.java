package org.sapotrace.pages;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Entry;
import org.sapotrace.refusal.Refusal;

/**
 * A form for one result, with what was typed into it. What is refused is said at its field, which
 * is named like the JSON pointer of what it stands for.
 */
public abstract sealed class EntryForm permits TitrationForm, ValueForm {

  private static final Pattern NUMBERED = Pattern.compile("([a-z]+)\\.(\\d+)\\.?.*");

  /**
   * One thing that is wrong, as it is told above the form.
   *
   * @param field the field it is about; null for more than one
   */
  public record Fault(@Nullable String field, String place, String message) {}

  private final Typed typed;
  private final SampleFields sample;

  EntryForm(Typed typed, SampleFields sample) {
    this.typed = typed;
    this.sample = sample;
  }

  Typed typed() {
    return typed;
  }

  SampleFields sampleFields() {
    return sample;
  }

  /** Batch and time of sampling. */
  public List<Field> sample() {
    return sample.fields(typed);
  }

  /** The offset of another clock than the one on the wall. */
  public Field offset() {
    return sample.offset(typed);
  }

  /** Every field but those of the sample and of a correction, in the order of the page. */
  abstract Stream<Field> fieldsOfEntry();

  private Stream<Field> fields() {
    return Stream.of(sample().stream(), Stream.of(offset()), fieldsOfEntry(), Stream.of(reason()))
        .flatMap(each -> each);
  }

  /** What was typed, as an entry; null where something is wrong with it, which is then told. */
  abstract @Nullable Entry read();

  /** The number on the page of what stands at a place among those that were read. */
  abstract int numberOf(int index);

  /** Why a result is corrected; on the page of a correction only. */
  public Field reason() {
    return Field.of(TitrationFields.REASON, "Why is it corrected?", Field.Kind.NEEDED_TEXT)
        .filled(typed);
  }

  String readReason() {
    return typed.needed(
        TitrationFields.REASON, 1000, "Say why: it stays on record beside what was there before.");
  }

  /** All that is wrong, in the order of the page. */
  public List<Fault> faults() {
    return Stream.concat(
            typed.faultsOfAll().stream().map(message -> new Fault(null, "", message)),
            fields()
                .filter(Field::isFaulty)
                .map(
                    field ->
                        new Fault(
                            field.name(), place(field), Objects.requireNonNull(field.fault()))))
        .toList();
  }

  /** The field in which a number stands, such as {@code Titration 2, sample}. */
  private static String place(Field field) {
    Matcher numbered = NUMBERED.matcher(field.name());
    return numbered.matches() && numbered.group(1).equals("replicates")
        ? "Titration " + numbered.group(2) + ", " + lowerCase(field.label())
        : field.label();
  }

  private static String lowerCase(String label) {
    return Character.toLowerCase(label.charAt(0)) + label.substring(1);
  }

  /** Says what was refused at the fields it is about. */
  void refuse(Refusal refusal) {
    refusal.faults().forEach(this::refuse);
  }

  private void refuse(Refusal.Fault fault) {
    String pointer = fault.pointer();
    Optional<String> field = pointer == null ? Optional.empty() : fieldAt(pointer);
    field.ifPresentOrElse(
        name -> typed.fault(name, fault.detail()), () -> typed.faultOfAll(fault.detail()));
  }

  /** The field that a pointer leads to, or the first of those that it leads to together. */
  private Optional<String> fieldAt(String pointer) {
    String[] steps = pointer.replaceFirst("^#?/", "").split("/", -1);
    for (int i = 0; i < steps.length; i++) {
      if (steps[i].matches("\\d{1,4}")) {
        steps[i] = String.valueOf(numberOf(Integer.parseInt(steps[i])));
      }
    }
    String name = String.join(".", steps);
    List<String> names = fields().map(Field::name).toList();
    return names.stream()
        .filter(name::equals)
        .findFirst()
        .or(
            () ->
                steps.length == 1
                    ? Optional.empty()
                    : names.stream().filter(each -> each.startsWith(name + ".")).findFirst());
  }
}
