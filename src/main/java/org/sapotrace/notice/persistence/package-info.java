/** Subscriptions, notices and their deliveries in PostgreSQL. */
@NullMarked
package org.sapotrace.notice.persistence;

import org.jspecify.annotations.NullMarked;
