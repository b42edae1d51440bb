/** What is stored of forecasts. */
@NullMarked
package org.sapotrace.forecast.persistence;

import org.jspecify.annotations.NullMarked;
