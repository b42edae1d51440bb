/** Keys over HTTP. */
@NullMarked
package org.sapotrace.access.rest;

import org.jspecify.annotations.NullMarked;
