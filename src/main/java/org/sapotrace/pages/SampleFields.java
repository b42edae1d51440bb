package org.sapotrace.pages;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Batch and time of sampling, which every entry has.
 *
 * @param clock by which times are typed
 * @param before when the sample was taken by what is on record, which is kept to the second unless
 *     another time is typed; null for a new sample
 * @param now for the name of the clock
 */
record SampleFields(WallClock clock, @Nullable Instant before, Instant now) {

  List<Field> fields(Typed typed) {
    return TitrationFields.sample(clock.name(before == null ? now : before)).stream()
        .map(field -> field.filled(typed))
        .toList();
  }

  Field offset(Typed typed) {
    return TitrationFields.offset().filled(typed);
  }

  void fill(Typed typed, String batch, Instant sampledAt) {
    typed.put(TitrationFields.BATCH, batch);
    typed.put(TitrationFields.SAMPLED_AT, clock.typed(sampledAt));
  }

  static String batch(Typed typed) {
    return typed.needed(TitrationFields.BATCH, 100, "Say which batch was sampled.");
  }

  @Nullable Instant sampledAt(Typed typed) {
    String field = TitrationFields.SAMPLED_AT;
    if (!typed.has(field)) {
      typed.fault(field, "Say when the sample was taken.");
      return null;
    }
    if (typed.has(TitrationFields.OFFSET)) {
      ZoneOffset offset = typed.read(TitrationFields.OFFSET, WallClock::offset);
      return offset == null ? null : typed.read(field, text -> WallClock.moment(text, offset));
    }
    if (before != null && typed.text(field).equals(clock.typed(before))) {
      return before;
    }
    try {
      return clock.moment(typed.text(field));
    } catch (WallClock.HourTwice needsOffset) {
      typed.fault(TitrationFields.OFFSET, String.valueOf(needsOffset.getMessage()));
    } catch (IllegalArgumentException noTime) {
      typed.fault(field, String.valueOf(noTime.getMessage()));
    }
    return null;
  }
}
