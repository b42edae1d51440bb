package org.sapotrace.http;

import jakarta.interceptor.InterceptorBinding;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * A POST that records: sent again with the same {@code Idempotency-Key} it is answered as the first
 * time and recorded no second time. What it records commits together with the answer, or not at
 * all. The method answers a {@link jakarta.ws.rs.core.Response}.
 */
@InterceptorBinding
@Target({ElementType.METHOD, ElementType.TYPE})
@Retention(RetentionPolicy.RUNTIME)
public @interface RecordsOnce {}
