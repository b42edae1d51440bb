/** The keys and accounts by which callers are known, and what each of them may do and touch. */
@NullMarked
package org.sapotrace.access;

import org.jspecify.annotations.NullMarked;
