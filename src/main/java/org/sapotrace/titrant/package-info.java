/** Titrant lots, their standardisations and what they were worth at any time. */
@NullMarked
package org.sapotrace.titrant;

import org.jspecify.annotations.NullMarked;
