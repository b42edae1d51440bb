/** People known by tokens of the plant's identity provider (OpenID Connect). */
@NullMarked
package org.sapotrace.access.oidc;

import org.jspecify.annotations.NullMarked;
