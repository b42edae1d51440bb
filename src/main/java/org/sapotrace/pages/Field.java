package org.sapotrace.pages;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One field of a form as it is shown.
 *
 * @param name in the form, made like the JSON pointer of what it stands for: {@code
 *     replicates.1.titrantMl}
 * @param label in words
 * @param unit shown beside it; null for none
 * @param hint what else to say of it; null for nothing
 * @param kind what is typed
 * @param options what there is to choose from, or to be reminded of where it is typed
 * @param text what stands in it
 * @param fault what is wrong with it; null for nothing
 */
public record Field(
    String name,
    String label,
    @Nullable String unit,
    @Nullable String hint,
    Kind kind,
    List<Option> options,
    String text,
    @Nullable String fault) {

  /** What is typed into a field. */
  public enum Kind {
    TEXT,
    NEEDED_TEXT,
    NUMBER,
    NEEDED_NUMBER,
    TIME,
    CHOICE
  }

  /** One of several to choose from. */
  public record Option(String value, String label) {}

  public Field {
    options = List.copyOf(options);
  }

  /** A text or a number, empty. */
  static Field of(String name, String label, Kind kind) {
    return new Field(name, label, null, null, kind, List.of(), "", null);
  }

  Field in(String unitBeside) {
    return new Field(name, label, unitBeside, hint, kind, options, text, fault);
  }

  Field hinting(String words) {
    return new Field(name, label, unit, words, kind, options, text, fault);
  }

  Field choosing(List<Option> among) {
    return new Field(name, label, unit, hint, Kind.CHOICE, among, text, fault);
  }

  Field suggesting(List<Option> some) {
    return new Field(name, label, unit, hint, kind, some, text, fault);
  }

  Field filled(Typed typed) {
    return new Field(name, label, unit, hint, kind, options, typed.text(name), typed.fault(name));
  }

  public boolean isFaulty() {
    return fault != null;
  }

  public boolean isEmpty() {
    return text.isEmpty();
  }

  public boolean isNumber() {
    return kind == Kind.NUMBER || kind == Kind.NEEDED_NUMBER;
  }

  public boolean isChoice() {
    return kind == Kind.CHOICE;
  }

  public boolean isTime() {
    return kind == Kind.TIME;
  }

  public boolean isNeeded() {
    return kind == Kind.TIME || kind == Kind.NEEDED_TEXT || kind == Kind.NEEDED_NUMBER;
  }

  /** The identifiers of all that describes the input. */
  public String describedBy() {
    StringBuilder ids = new StringBuilder();
    if (fault != null) {
      ids.append(name).append("-fault ");
    }
    if (unit != null) {
      ids.append(name).append("-unit ");
    }
    if (hint != null) {
      ids.append(name).append("-hint ");
    }
    return ids.toString().strip();
  }
}
