package org.sapotrace.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.IOException;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.FaultProxy;
import org.sapotrace.testing.ProxiedPostgresResource;

@QuarkusTest
@WithTestResource(ProxiedPostgresResource.class)
class IntakeWithoutDatabaseTest {

  private static final byte[] EVENT =
      """
      {"specversion": "1.0", "source": "urn:plant:titrator-2", "id": "1",
       "type": "org.sapotrace.result.measured", "data":
       {"batch": "K-0142", "sampledAt": "2026-03-04T09:20:00Z", "values": [31.2]}}
      """
          .getBytes(UTF_8);

  @Inject Intake intake;

  FaultProxy database;

  /** So it is not acknowledged, and the broker brings it again. */
  @Test
  void answersNothingUntilTheRecordIsThere() throws IOException {
    Topics.Place place = new Topics.Place(TestStream.soap().line, "watched");
    database.part();
    try {
      assertThatThrownBy(() -> intake.take(place, EVENT, false))
          .isInstanceOf(RuntimeException.class);
    } finally {
      database.join();
    }
    await()
        .ignoreExceptions()
        .untilAsserted(
            () -> assertThat(intake.take(place, EVENT, false).outcome()).isEqualTo("recorded"));
  }
}
