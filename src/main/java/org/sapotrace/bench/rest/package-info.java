/** Titrations, results and calculations over HTTP. */
@NullMarked
package org.sapotrace.bench.rest;

import org.jspecify.annotations.NullMarked;
