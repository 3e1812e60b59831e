//! The device's own voice.
//!
//! A voice that lives on the device is taken before one that asks a server, so that it speaks with no
//! network too. Where there is none, nothing is said and the screen says why.

use super::of;
use leptos::prelude::window;
use wasm_bindgen::JsCast;
use web_sys::{SpeechSynthesis, SpeechSynthesisUtterance, SpeechSynthesisVoice};

fn speech() -> Option<SpeechSynthesis> {
    of(&window(), "SpeechSynthesisUtterance")?;
    of(&window(), "speechSynthesis")?.dyn_into().ok()
}

/// The voice of a language, as `en-GB`, that is on the device itself; one of another country, if only
/// the language fits. None if the device has none (or hasn't told of it yet).
pub fn voice(language: &str) -> Option<SpeechSynthesisVoice> {
    let voices = speech()?.get_voices();
    let own = voices
        .iter()
        .filter_map(|voice| voice.dyn_into::<SpeechSynthesisVoice>().ok())
        .filter(SpeechSynthesisVoice::local_service);
    let (tongue, _) = language.split_once('-').unwrap_or((language, ""));
    // Some write `en_GB`.
    let fits = |voice: &SpeechSynthesisVoice| {
        let spoken = voice.lang().replace('_', "-");
        (spoken == language, spoken.starts_with(tongue))
    };
    own.map(|voice| (fits(&voice), voice))
        .filter(|((_, tongue), _)| *tongue)
        .max_by_key(|(fits, _)| *fits)
        .map(|(_, voice)| voice)
}

/// Says a text, in place of whatever is being said.
pub fn say(text: &str, language: &str) {
    let Some(speech) = speech() else { return };
    speech.cancel();
    if let Ok(utterance) = SpeechSynthesisUtterance::new_with_text(text) {
        utterance.set_lang(language);
        utterance.set_voice(voice(language).as_ref());
        speech.speak(&utterance);
    }
}

/// Falls silent.
pub fn hush() {
    if let Some(speech) = speech() {
        speech.cancel();
    }
}
