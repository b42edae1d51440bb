/** The lines and streams in PostgreSQL. */
@NullMarked
package org.sapotrace.productline.persistence;

import org.jspecify.annotations.NullMarked;
