/**
 * How long a control chart runs before it signals, and charts that run as wanted. Pure computation.
 */
@NullMarked
package org.sapotrace.runlength;

import org.jspecify.annotations.NullMarked;
