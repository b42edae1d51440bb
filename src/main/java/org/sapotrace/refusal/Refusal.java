package org.sapotrace.refusal;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * A request that was understood and is not carried out. The message is written for the person who
 * asked: it says what is wrong and what to do instead, and names no class and no table.
 *
 * <p>It is not a defect of the service; a defect is any other unchecked exception.
 */
public final class Refusal extends RuntimeException {

  private static final long serialVersionUID = 1L;

  /** Why a request is refused. */
  public enum Kind {
    /** It names something that is not there, or not for the one who asks. */
    UNKNOWN,
    /** The one who asks may look at what is to be changed, and not change it. */
    FORBIDDEN,
    /** It contradicts what is already recorded. */
    CONFLICT,
    /** The one who asks holds an outdated version of what is to be changed. */
    OUTDATED,
    /** It says something impossible, or too little. */
    IMPOSSIBLE,
    /** It asks for something that this version does not do. */
    NOT_YET
  }

  /**
   * One thing that is wrong.
   *
   * @param detail what is wrong, in words
   * @param pointer the JSON pointer of the field in the request, such as {@code
   *     #/replicates/1/titrantMl}; null where it is not about one field
   */
  public record Fault(String detail, @Nullable String pointer) {

    private Fault within(String field) {
      return pointer == null ? this : new Fault(detail, "#/" + field + pointer.substring(1));
    }
  }

  private final Kind kind;
  // Always set by the constructor; transient only because records of faults need not be serialised.
  private final transient List<Fault> faults;

  private Refusal(Kind kind, List<Fault> faults) {
    super(String.join(" ", faults.stream().map(Fault::detail).toList()));
    this.kind = kind;
    this.faults = List.copyOf(faults);
  }

  public static Refusal unknown(String detail) {
    return new Refusal(Kind.UNKNOWN, List.of(new Fault(detail, null)));
  }

  public static Refusal forbidden(String detail) {
    return new Refusal(Kind.FORBIDDEN, List.of(new Fault(detail, null)));
  }

  public static Refusal conflict(String detail) {
    return new Refusal(Kind.CONFLICT, List.of(new Fault(detail, null)));
  }

  public static Refusal outdated(String detail) {
    return new Refusal(Kind.OUTDATED, List.of(new Fault(detail, null)));
  }

  /** The request as a whole says something impossible. */
  public static Refusal impossible(String detail) {
    return new Refusal(Kind.IMPOSSIBLE, List.of(new Fault(detail, null)));
  }

  /** One field of the request, named by its JSON pointer, says something impossible. */
  public static Refusal impossible(String pointer, String detail) {
    return new Refusal(Kind.IMPOSSIBLE, List.of(new Fault(detail, pointer)));
  }

  /**
   * Several things are impossible.
   *
   * @param faults at least one
   */
  public static Refusal impossible(List<Fault> faults) {
    return new Refusal(Kind.IMPOSSIBLE, faults);
  }

  /** One field of the request, named by its JSON pointer, asks for what is not built yet. */
  public static Refusal notYet(String pointer, String detail) {
    return new Refusal(Kind.NOT_YET, List.of(new Fault(detail, pointer)));
  }

  /**
   * The value, or a refusal that points at the field when computing it fails because the field is
   * out of range.
   *
   * @param pointer the JSON pointer of the field
   * @param value computes the value and throws {@link IllegalArgumentException}, with a message fit
   *     for the one who asked, where it cannot be had
   */
  public static <T> T at(String pointer, Supplier<T> value) {
    try {
      return value.get();
    } catch (IllegalArgumentException outOfRange) {
      throw impossible(pointer, String.valueOf(outOfRange.getMessage()));
    }
  }

  /**
   * Carries out several checks, each of which may refuse, and refuses with the faults of all.
   *
   * @throws Refusal of the kind of the first, if any of them refuses
   */
  public static void together(Runnable... checks) {
    List<Refusal> refused = new ArrayList<>();
    for (Runnable check : checks) {
      try {
        check.run();
      } catch (Refusal refusal) {
        refused.add(refusal);
      }
    }
    if (!refused.isEmpty()) {
      throw new Refusal(
          refused.get(0).kind, refused.stream().flatMap(each -> each.faults.stream()).toList());
    }
  }

  /**
   * The value, or a refusal whose pointers lead through the field in which the rest of the request
   * lies.
   *
   * @param field the field's name
   * @param value computes the value, refusing as if the field were the whole request
   */
  public static <T> T within(String field, Supplier<T> value) {
    try {
      return value.get();
    } catch (Refusal refusal) {
      throw new Refusal(
          refusal.kind, refusal.faults.stream().map(fault -> fault.within(field)).toList());
    }
  }

  public Kind kind() {
    return kind;
  }

  /** What is wrong, one entry for each thing; never empty. */
  public List<Fault> faults() {
    return faults;
  }
}
