/** Control charts of the streams: limits, the judgement of each new result, and signals. */
@NullMarked
package org.sapotrace.monitoring;

import org.jspecify.annotations.NullMarked;
