/**
 * The PostgreSQL that comes with the service, for a bench that has none: durable, on loopback only,
 * never without a password, and gone from the process table when the service is.
 */
@NullMarked
package org.sapotrace.embedded;

import org.jspecify.annotations.NullMarked;
