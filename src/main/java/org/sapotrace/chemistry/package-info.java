/** What a titration says about a sample, how sure that is, and what follows. Pure computation. */
@NullMarked
package org.sapotrace.chemistry;

import org.jspecify.annotations.NullMarked;
