package org.sapotrace.monitoring;

import java.util.UUID;

/**
 * A result that was left out of a baseline.
 *
 * @param cause why, in somebody's words
 */
public record Exclusion(UUID result, String cause) {}
