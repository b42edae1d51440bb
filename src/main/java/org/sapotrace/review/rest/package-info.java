/** The review document over HTTP. */
@NullMarked
package org.sapotrace.review.rest;

import org.jspecify.annotations.NullMarked;
