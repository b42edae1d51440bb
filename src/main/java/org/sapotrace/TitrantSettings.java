package org.sapotrace;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Produces;
import jakarta.inject.Singleton;
import org.eclipse.microprofile.config.Config;
import org.sapotrace.refusal.Refusal;
import org.sapotrace.titrant.StandardisationValidity;

/** What is set about titrants. */
@ApplicationScoped
class TitrantSettings {

  private final Config settings;

  TitrantSettings(Config settings) {
    this.settings = settings;
  }

  @Produces
  @Singleton
  StandardisationValidity standardisationValidity() {
    return standardisationValidity(settings);
  }

  /**
   * How long a standardisation counts without a caution, as {@code
   * SAPOTRACE_STANDARDISATION_VALID_FOR} says.
   *
   * @throws Refusal for what is no such duration
   */
  static StandardisationValidity standardisationValidity(Config settings) {
    return StandardisationValidity.of(
        settings
            .getOptionalValue("sapotrace.standardisation-valid-for", String.class)
            .orElse(StandardisationValidity.DEFAULT));
  }
}
