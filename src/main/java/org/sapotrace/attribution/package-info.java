/**
 * What moved: the titrant, the blank, the wash or the feed, estimated from all that was titrated.
 */
@NullMarked
package org.sapotrace.attribution;

import org.jspecify.annotations.NullMarked;
