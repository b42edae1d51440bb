package org.sapotrace;

import io.quarkus.runtime.StartupEvent;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Singleton;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneOffset;
import org.eclipse.microprofile.config.Config;
import org.sapotrace.demonstration.DemonstrationPlant;

/**
 * Fills an empty database with the demonstration plant, where that is wanted, before requests are
 * answered. Whoever starts the service again with the same settings finds it as they left it.
 */
@Singleton
class Demonstration {

  private static final int TELLING_EVERY = 26;

  private final Config settings;
  private final DemonstrationPlant plant;
  private final InstantSource clock;

  Demonstration(Config settings, DemonstrationPlant plant, InstantSource clock) {
    this.settings = settings;
    this.plant = plant;
    this.clock = clock;
  }

  void fill(@Observes StartupEvent start) {
    if (!DemonstrationSettings.isWanted(settings)) {
      return;
    }
    switch (plant.state()) {
      case NOTHING_AT_ALL -> fill();
      case SOMETHING ->
          say("The database is not empty, so that the demonstration plant is left as it is.");
      case BEGUN_AND_NOT_FINISHED ->
          say(
              "The demonstration plant in this database is not complete, as somebody stopped its"
                  + " filling: start on an empty database to have all of it.");
    }
  }

  /** It ends yesterday, so that nothing of it lies ahead. */
  private void fill() {
    Instant begun = clock.instant();
    LocalDate yesterday = LocalDate.ofInstant(begun, ZoneOffset.UTC).minusDays(1);
    plant.fill(yesterday, this::tell);
    say(
        "The demonstration plant is filled in, which took %d s."
            .formatted(Duration.between(begun, clock.instant()).toSeconds()));
  }

  private void tell(int days) {
    if (days % TELLING_EVERY == 0) {
      say("Demonstration plant: %d of %d days.".formatted(days, DemonstrationPlant.DAYS));
    }
  }

  /** On the standard output, for whoever waits at the start. */
  private static void say(String sentence) {
    System.out.println(sentence);
  }
}
