/** How far a process in control stays from its specification limits. Pure computation. */
@NullMarked
package org.sapotrace.capability;

import org.jspecify.annotations.NullMarked;
