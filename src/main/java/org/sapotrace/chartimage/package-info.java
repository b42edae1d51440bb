/** Pictures of control charts, and papers with them: the only package that knows how to draw. */
@NullMarked
package org.sapotrace.chartimage;

import org.jspecify.annotations.NullMarked;
