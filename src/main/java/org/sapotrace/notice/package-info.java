/**
 * Tells others what happened: subscriptions, what is to be told, its delivery and the live feed.
 */
@NullMarked
package org.sapotrace.notice;

import org.jspecify.annotations.NullMarked;
