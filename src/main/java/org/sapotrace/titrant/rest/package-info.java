/** Titrant lots and standardisations over HTTP. */
@NullMarked
package org.sapotrace.titrant.rest;

import org.jspecify.annotations.NullMarked;
