/** Control charts: constants, limits, run rules and the data of a picture. Pure computation. */
@NullMarked
package org.sapotrace.controlchart;

import org.jspecify.annotations.NullMarked;
