package org.sapotrace.webhook;

import java.net.URI;
import java.time.Instant;
import java.util.List;
import java.util.stream.Collectors;

/**
 * What is sent.
 *
 * @param id the same each time it is sent
 * @param sentAt when it is sent this time
 * @param body JSON of a CloudEvent
 * @param secrets to sign by; more than one while a new secret takes over from an old one
 */
public record Message(URI target, String id, Instant sentAt, String body, List<Secret> secrets) {

  public Message {
    secrets = List.copyOf(secrets);
  }

  /** The signatures, one for each secret. */
  String signatures() {
    return secrets.stream()
        .map(secret -> secret.sign(id, sentAt, body))
        .collect(Collectors.joining(" "));
  }
}
