/** Publishes notices to an MQTT broker, and takes results from it, where one is configured. */
@NullMarked
package org.sapotrace.mqtt;

import org.jspecify.annotations.NullMarked;
