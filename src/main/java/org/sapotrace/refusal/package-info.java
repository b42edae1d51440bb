/**
 * What the service will not do, and why, in words for whoever asked. Below every other package, so
 * that each of them can refuse without knowing how the refusal travels.
 */
@NullMarked
package org.sapotrace.refusal;

import org.jspecify.annotations.NullMarked;
