/** What streams are heading for, and what moved behind a signal. */
@NullMarked
package org.sapotrace.forecast;

import org.jspecify.annotations.NullMarked;
