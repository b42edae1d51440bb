/** Writes all that is on record into one file, and reads it back into an empty database. */
@NullMarked
package org.sapotrace.backup;

import org.jspecify.annotations.NullMarked;
