/** Subscriptions, their deliveries and the live feed over HTTP. */
@NullMarked
package org.sapotrace.notice.rest;

import org.jspecify.annotations.NullMarked;
