/** What a wash, a tower, a flush or a tank is heading for, with an interval. Pure computation. */
@NullMarked
package org.sapotrace.washmodel;

import org.jspecify.annotations.NullMarked;
