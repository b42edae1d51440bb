/** The pages for people at the bench: plain HTML that needs no script. */
@NullMarked
package org.sapotrace.pages;

import org.jspecify.annotations.NullMarked;
