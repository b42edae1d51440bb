/** The ledger in PostgreSQL. */
@NullMarked
package org.sapotrace.ledger.persistence;

import org.jspecify.annotations.NullMarked;
