/**
 * Quantities with their ranges, values with their uncertainty, and the budget. Pure computation.
 */
@NullMarked
package org.sapotrace.measure;

import org.jspecify.annotations.NullMarked;
