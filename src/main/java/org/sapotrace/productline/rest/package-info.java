/** Lines and streams over HTTP. */
@NullMarked
package org.sapotrace.productline.rest;

import org.jspecify.annotations.NullMarked;
