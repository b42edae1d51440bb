package org.sapotrace.http;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.ser.std.StdScalarSerializer;
import java.io.IOException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;

/** Writers of single JSON values. */
final class PlainValue {

  private PlainValue() {}

  /** To the microsecond, which is what the database keeps: the same before and after storing. */
  static final class Moment extends StdScalarSerializer<Instant> {
    private static final long serialVersionUID = 1L;

    Moment() {
      super(Instant.class);
    }

    @Override
    public void serialize(Instant moment, JsonGenerator json, SerializerProvider provider)
        throws IOException {
      json.writeString(moment.truncatedTo(ChronoUnit.MICROS).toString());
    }
  }

  /** JSON has no NaN: a number that is not there is null, never the text "NaN". */
  static final class FiniteNumber extends StdScalarSerializer<Double> {
    private static final long serialVersionUID = 1L;

    FiniteNumber(Class<Double> type) {
      super(type);
    }

    @Override
    public void serialize(Double value, JsonGenerator json, SerializerProvider provider)
        throws IOException {
      if (Double.isFinite(value)) {
        json.writeNumber(value);
      } else {
        json.writeNull();
      }
    }
  }
}
