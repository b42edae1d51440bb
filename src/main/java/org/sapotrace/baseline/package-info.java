/** What a baseline says about itself before limits are taken from it. Pure computation. */
@NullMarked
package org.sapotrace.baseline;

import org.jspecify.annotations.NullMarked;
