/** Pictures of control charts: the only package that knows how a chart is drawn. */
@NullMarked
package org.sapotrace.chartimage;

import org.jspecify.annotations.NullMarked;
