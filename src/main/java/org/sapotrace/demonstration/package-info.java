/** An invented plant whose faults are known, recorded through the same services as a real one. */
@NullMarked
package org.sapotrace.demonstration;

import org.jspecify.annotations.NullMarked;
