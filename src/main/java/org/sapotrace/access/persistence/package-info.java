/** The keys in PostgreSQL. */
@NullMarked
package org.sapotrace.access.persistence;

import org.jspecify.annotations.NullMarked;
