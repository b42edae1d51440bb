package org.sapotrace.mqtt;

import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import com.fasterxml.jackson.databind.JsonNode;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Pattern;
import org.sapotrace.http.SafeText;

/**
 * A result as a CloudEvent of version 1.0, in structured mode; further attributes are nobody's
 * fault (CloudEvents 1.0.2, "Extension Context Attributes").
 *
 * @param source with {@code id} the name of the event: what has both in common is the same event
 * @param data a titration or a result, as the interface takes it
 */
@JsonIgnoreProperties(ignoreUnknown = true)
record ResultEvent(
    @NotNull @Pattern(regexp = "1\\.0", message = "must be 1.0") String specversion,
    @NotNull @SafeText(max = 255) String source,
    @NotNull @SafeText(max = 255) String id,
    @NotNull
        @Pattern(
            regexp = "org\\.sapotrace\\.result\\.measured",
            message = "must be org.sapotrace.result.measured")
        String type,
    @NotNull JsonNode data) {}
