package org.sapotrace;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Produces;
import jakarta.inject.Singleton;
import org.eclipse.microprofile.config.Config;
import org.sapotrace.forecast.ForecastHorizon;
import org.sapotrace.refusal.Refusal;

/** What is set about forecasts. */
@ApplicationScoped
class ForecastSettings {

  private final Config settings;

  ForecastSettings(Config settings) {
    this.settings = settings;
  }

  @Produces
  @Singleton
  ForecastHorizon horizon() {
    return horizon(settings);
  }

  /**
   * How far ahead a crossing is told, as {@code SAPOTRACE_FORECAST_HORIZON} says.
   *
   * @throws Refusal for what is no such duration
   */
  static ForecastHorizon horizon(Config settings) {
    return ForecastHorizon.of(
        settings
            .getOptionalValue("sapotrace.forecast-horizon", String.class)
            .orElse(ForecastHorizon.DEFAULT));
  }
}
