# Der Landungseintrag.
