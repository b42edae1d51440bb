/** Product lines and their streams: what is made, where it is sampled and what it must meet. */
@NullMarked
package org.sapotrace.productline;

import org.jspecify.annotations.NullMarked;
