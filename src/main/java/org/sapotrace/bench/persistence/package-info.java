/** Results in PostgreSQL. */
@NullMarked
package org.sapotrace.bench.persistence;

import org.jspecify.annotations.NullMarked;
