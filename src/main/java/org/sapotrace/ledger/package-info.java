/**
 * The append-only record of who changed what, chain by chain, and whether it is still as it was
 * written.
 */
@NullMarked
package org.sapotrace.ledger;

import org.jspecify.annotations.NullMarked;
