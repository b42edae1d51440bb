/** The review document: what the record says of a line in a period, for whoever asks afterwards. */
@NullMarked
package org.sapotrace.review;

import org.jspecify.annotations.NullMarked;
