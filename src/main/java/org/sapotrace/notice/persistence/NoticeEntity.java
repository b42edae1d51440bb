package org.sapotrace.notice.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.NullUnmarked;
import org.sapotrace.notice.Notice;
import org.sapotrace.notice.Outbox;

@Entity
@Table(name = "notice")
@NullUnmarked
class NoticeEntity {

  @Embeddable
  record Key(@Column(name = "stream_id") UUID streamId, UUID id) {}

  @EmbeddedId Key key;
  String line;
  String type;
  UUID about;

  @Column(name = "recorded_at")
  Instant recordedAt;

  String event;
  Long number;

  static NoticeEntity of(Notice notice, String event) {
    NoticeEntity entity = new NoticeEntity();
    entity.key = new Key(notice.stream(), notice.id());
    entity.line = notice.line();
    entity.type = notice.type().id();
    entity.about = notice.about();
    entity.recordedAt = notice.at();
    entity.event = event;
    return entity;
  }

  Outbox.Numbered toNumbered() {
    return new Outbox.Numbered(number, type, event);
  }
}
