/**
 * How the service speaks HTTP, whatever it speaks about: problem details, what JSON is taken, pages
 * of lists, conditional requests and the guard at the door. Knows no word of the domain.
 *
 * <p>Enumerations travel by their id: an enum with a method {@code public String id()} is written,
 * read and taken as a parameter by what that method answers, with no annotation, so that pure
 * packages need not know JSON. Any other enum travels by the names of its constants.
 *
 * <p>A request body is a record whose numbers are {@code Double}, {@code Integer} or {@code Long}
 * with {@code @NotNull} where they are required, and whose lists are {@code List}, never arrays:
 * the checks of every number and text in {@link org.sapotrace.http.StrictJson} see those.
 */
@NullMarked
package org.sapotrace.http;

import org.jspecify.annotations.NullMarked;
