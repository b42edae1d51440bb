package org.sapotrace.http;

import com.fasterxml.jackson.databind.cfg.MapperConfig;
import com.fasterxml.jackson.databind.introspect.AnnotatedClass;
import com.fasterxml.jackson.databind.introspect.NopAnnotationIntrospector;
import java.lang.reflect.Method;
import java.util.LinkedHashMap;
import java.util.Map;

/** Gives the constants of an enum the names by which they travel: their {@code id()}. */
final class EnumIds extends NopAnnotationIntrospector {

  private static final long serialVersionUID = 1L;

  @Override
  public String[] findEnumValues(
      MapperConfig<?> config, AnnotatedClass type, Enum<?>[] constants, String[] names) {
    for (int i = 0; i < constants.length; i++) {
      String id = id(constants[i]);
      // A name that an annotation has already given stays.
      names[i] = id.equals(constants[i].name()) ? names[i] : id;
    }
    return names;
  }

  /** The constants of an enum by the names by which they travel, in their declared order. */
  static <T> Map<String, T> of(Class<T> type) {
    Map<String, T> constants = new LinkedHashMap<>();
    for (T constant : type.getEnumConstants()) {
      constants.put(id((Enum<?>) constant), constant);
    }
    return constants;
  }

  private static String id(Enum<?> constant) {
    try {
      Method id = constant.getDeclaringClass().getMethod("id");
      id.trySetAccessible();
      return id.getReturnType() == String.class ? (String) id.invoke(constant) : constant.name();
    } catch (NoSuchMethodException without) {
      return constant.name();
    } catch (ReflectiveOperationException failed) {
      throw new IllegalStateException("The id of " + constant + " cannot be had", failed);
    }
  }
}
