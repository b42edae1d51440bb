/** Titrant lots in PostgreSQL. */
@NullMarked
package org.sapotrace.titrant.persistence;

import org.jspecify.annotations.NullMarked;
