/** Forecasts and attributions over HTTP. */
@NullMarked
package org.sapotrace.forecast.rest;

import org.jspecify.annotations.NullMarked;
