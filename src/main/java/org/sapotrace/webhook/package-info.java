/** Signed messages to receivers elsewhere, sent only to where they may go. */
@NullMarked
package org.sapotrace.webhook;

import org.jspecify.annotations.NullMarked;
