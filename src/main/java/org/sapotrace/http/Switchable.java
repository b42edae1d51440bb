package org.sapotrace.http;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.BeanProperty;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.JavaType;
import com.fasterxml.jackson.databind.JsonDeserializer;
import com.fasterxml.jackson.databind.annotation.JsonDeserialize;
import com.fasterxml.jackson.databind.deser.ContextualDeserializer;
import com.fasterxml.jackson.databind.deser.std.StdDeserializer;
import java.io.IOException;
import org.jspecify.annotations.Nullable;

/**
 * A setting of a request that may be left out, switched off by null, or given: three things of
 * which plain fields make two. A field of this type is itself null where the setting was left out.
 *
 * @param value what was given; null where it was switched off
 */
@JsonDeserialize(using = Switchable.Reader.class)
public record Switchable<T>(@Nullable T value) {

  static final class Reader extends StdDeserializer<Switchable<?>>
      implements ContextualDeserializer {
    private static final long serialVersionUID = 1L;
    private final @Nullable JavaType content;

    Reader() {
      this(null);
    }

    private Reader(@Nullable JavaType content) {
      super(Switchable.class);
      this.content = content;
    }

    @Override
    public JsonDeserializer<?> createContextual(
        DeserializationContext context, @Nullable BeanProperty property) {
      JavaType type = property == null ? context.getContextualType() : property.getType();
      return new Reader(type.containedType(0));
    }

    @Override
    public Switchable<?> deserialize(JsonParser parser, DeserializationContext context)
        throws IOException {
      return new Switchable<>(context.readValue(parser, content));
    }

    @Override
    public Switchable<?> getNullValue(DeserializationContext context) {
      return new Switchable<>(null);
    }

    @Override
    public @Nullable Object getAbsentValue(DeserializationContext context) {
      return null;
    }
  }
}
