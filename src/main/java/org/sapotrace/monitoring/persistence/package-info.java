/** Charts, limits and signals in PostgreSQL. */
@NullMarked
package org.sapotrace.monitoring.persistence;

import org.jspecify.annotations.NullMarked;
