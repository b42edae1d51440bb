/** Titrations and results as they were entered, and what was made of them. */
@NullMarked
package org.sapotrace.bench;

import org.jspecify.annotations.NullMarked;
