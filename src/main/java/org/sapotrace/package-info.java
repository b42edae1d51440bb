/** Sapotrace: soap titrations of biodiesel, their uncertainty, verdicts and control charts. */
@NullMarked
package org.sapotrace;

import org.jspecify.annotations.NullMarked;
