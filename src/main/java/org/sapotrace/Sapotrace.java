package org.sapotrace;

import io.quarkus.runtime.Application;
import io.quarkus.runtime.Quarkus;
import io.quarkus.runtime.annotations.QuarkusMain;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.config.Config;
import org.eclipse.microprofile.config.ConfigProvider;
import org.sapotrace.embedded.EmbeddedDatabase;
import org.sapotrace.refusal.Refusal;

/**
 * Starts the service, with a PostgreSQL of its own where no other is configured.
 *
 * <p>Ends with status 1 and one sentence on the standard error where it refuses to start, and stops
 * its PostgreSQL after the last request is answered.
 */
@QuarkusMain
public final class Sapotrace {

  static final String JDBC_URL = "quarkus.datasource.jdbc.url";

  Sapotrace() {}

  /**
   * Runs the service until it is told to stop; or does an {@link Errand} instead.
   *
   * @param arguments of an errand, {@code --demo}, or none
   */
  public static void main(String... arguments) {
    Config settings = ConfigProvider.getConfig();
    try {
      Errand.Asked errand = Errand.of(List.of(arguments));
      if (errand != null) {
        System.exit(ErrandRun.of(errand, settings));
      }
      read(arguments);
      DemonstrationSettings.isWanted(settings);
      AccessSettings.check(settings);
      ListeningPort.check(settings);
      TitrantSettings.standardisationValidity(settings);
      ForecastSettings.horizon(settings);
      NoticeConfiguration.check(settings);
      MqttConfiguration.mqttSettings(settings);
      Optional<String> url = settings.getOptionalValue(JDBC_URL, String.class);
      if (url.isPresent()) {
        ExistingDatabase.check(url.get(), settings);
      } else {
        startDatabase(dataDirectory(settings));
      }
    } catch (Refusal refused) {
      System.err.println("Sapotrace does not start. " + refused.getMessage());
      System.exit(1);
    }
    Quarkus.run(arguments);
  }

  private static void read(String[] arguments) {
    for (String argument : arguments) {
      if (!argument.equals("--demo")) {
        throw Refusal.impossible(
            """
            The argument "%s" is unknown: --demo, --backup FILE, --restore FILE and \
            --verify-ledger are known. Sapotrace is configured by environment variables."""
                .formatted(argument));
      }
      System.setProperty(DemonstrationSettings.WANTED, "true");
    }
  }

  static Path dataDirectory(Config settings) {
    return settings
        .getOptionalValue("sapotrace.data.directory", String.class)
        .map(Path::of)
        .orElseGet(
            () ->
                Optional.ofNullable(System.getenv("XDG_DATA_HOME"))
                    .filter(home -> !home.isEmpty())
                    .map(Path::of)
                    .orElse(Path.of(System.getProperty("user.home"), ".local", "share"))
                    .resolve("sapotrace"));
  }

  private static void startDatabase(Path directory) {
    EmbeddedDatabase database = EmbeddedDatabase.start(directory);
    Runtime.getRuntime().addShutdownHook(new Thread(() -> stop(database), "database"));
    System.setProperty(JDBC_URL, database.jdbcUrl());
    System.setProperty("quarkus.datasource.username", database.username());
    System.setProperty("quarkus.datasource.password", database.password());
    ReadyLine.dataIn(directory.toAbsolutePath().normalize().toString());
  }

  /** Hooks run side by side, so this one first waits for the service to have stopped. */
  private static void stop(EmbeddedDatabase database) {
    Application service = Application.currentApplication();
    if (service != null) {
      service.stop();
    }
    try {
      database.close();
    } catch (Refusal refused) {
      System.err.println(refused.getMessage());
    }
  }
}
