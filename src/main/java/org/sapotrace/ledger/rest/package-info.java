/** The ledger over HTTP. */
@NullMarked
package org.sapotrace.ledger.rest;

import org.jspecify.annotations.NullMarked;
