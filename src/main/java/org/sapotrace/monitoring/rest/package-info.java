/** Limits, charts and signals over HTTP. */
@NullMarked
package org.sapotrace.monitoring.rest;

import org.jspecify.annotations.NullMarked;
